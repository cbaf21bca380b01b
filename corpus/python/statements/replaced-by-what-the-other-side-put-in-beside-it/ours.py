def draw(board, level, rows):
    log("drawn")
    assert level
    assert rows
    board.flush()
