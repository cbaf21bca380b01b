def moor(board):
    level = draw(44)
    publish(board, level)
    store(board, "tide")
    return level
