def publish(board, level):
    """Shows a level to everybody."""
    board.show(level)
    board.journal.write(level)
    board.last = level
