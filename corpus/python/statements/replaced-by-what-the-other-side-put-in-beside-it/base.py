def draw(board, level, rows):
    log("drawn")
    assert level
    board.flush()
