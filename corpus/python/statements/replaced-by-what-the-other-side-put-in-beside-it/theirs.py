def draw(board, level, rows):
    log("drawn")
    assert rows
    board.flush()
