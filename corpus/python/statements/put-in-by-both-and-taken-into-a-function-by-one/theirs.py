def moor(board):
    finish(board)
    return level


def finish(board):
    level = draw(44)
    publish(board, level)
    store(board, "tide")
