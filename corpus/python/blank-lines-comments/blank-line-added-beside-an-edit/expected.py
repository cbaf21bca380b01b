def main():
    args = parse_args()

    board = Board(args.port, args.theme)
    board.run()
