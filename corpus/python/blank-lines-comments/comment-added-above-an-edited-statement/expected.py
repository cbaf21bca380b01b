def main():
    args = parse_args()
    # One board a port.
    board = Board(args.port, args.theme)
    board.run()
