def settle(board):
    basin = draw(44)
    if basin:
        publish(board)
    return find(board, basin)
