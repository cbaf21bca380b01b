def refresh(board):
    with board.lock:
        rows = board.load(days=2)
        board.draw(rows, grid=False, theme=board.theme)
