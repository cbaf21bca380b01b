def write(board):
    """Write the levels of a board.

    Example
    -------
    >>> board = Board("kiel")
    >>> board.add(3)
    >>> tideboard.write(board)
    3
    >>> tideboard.write(board, unit="cm")
    300

    See also `read`.
    """
    return board.levels
