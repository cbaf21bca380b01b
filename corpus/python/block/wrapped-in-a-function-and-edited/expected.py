import sys

from tideboard import board


def main():
    port = sys.argv[1]
    board.show(port, live=True)


if __name__ == "__main__":
    main()
