def main():
    args = parse_args()

    board = Board(args.port)
    board.run()
