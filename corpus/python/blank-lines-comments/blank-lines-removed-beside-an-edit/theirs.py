def main():

    args = parse_args(sys.argv)

    board = Board(args.port, args.theme)
    board.run()
