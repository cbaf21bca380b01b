def refresh(board):
    global shown, lamp, level
    level = board.level
    shown = board
    lamp = board.lamp
