def main():
    args = parse_args()
    board = Board(args.port)
    # Returns when the window is closed.
    board.run()
