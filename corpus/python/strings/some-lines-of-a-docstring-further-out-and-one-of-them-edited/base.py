def write(board):
    """Write the levels of a board.

    Example:
        >>> board = Board("kiel")
        >>> board.add(3)
        >>> write(board)
        3
        >>> write(board, unit="cm")
        300

    See also `read`.
    """
    return board.levels
