def refresh(board):
    global shown, level
    level = board.level
    shown = board
