def refresh(board):
    if board.visible:
        rows = board.load()
        board.draw(rows)
