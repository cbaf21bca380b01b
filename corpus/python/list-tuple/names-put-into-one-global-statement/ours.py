def refresh(board):
    global shown, lamp
    shown = board
    lamp = board.lamp
