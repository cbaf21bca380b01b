def refresh(board):
    global shown
    shown = board
