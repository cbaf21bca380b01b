def main():
    args = parse_args()
    board = Board(args.port)
    board.load()
    # Returns when the window is closed.
    board.run()
