def main():
    args = parse_args()
    board = Board(args.port)
    board.load()
    board.run()
