def publish(board, level):
    """Shows a level to everybody."""
    if board.ready:
        board.show(level)
        board.journal.write(level)
    board.last = level
    return board.visitors
