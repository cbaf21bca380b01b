def settle(board):
    level = draw(44)
    if level:
        publish(board)
    return find(board, level)
