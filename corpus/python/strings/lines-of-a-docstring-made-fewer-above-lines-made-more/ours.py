def hashes(board):
    """Return the hashes of a board.

    >>> board.add_rows([(1, 3), (2, 3), (1, 6)])
    >>> first = hashes(board, rounds=3, size=8)
    >>> second = hashes(board, rounds=4, size=8)

    They are short.
    """
    return board.hashes
