def refresh(board):
    global shown, level, lamp
    level = board.level
    shown = board
    lamp = board.lamp
