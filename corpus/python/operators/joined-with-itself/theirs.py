def settle(board):
    basin = draw(44)
    if basin and level:
        publish(board)
    return find(board, basin)
