def moor(board):
    level = draw(44)
    publish(board, level)
    return level
