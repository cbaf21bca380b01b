def settle(board):
    basin = draw(44)
<<<<<<< ours
    if basin:
=======
    if basin and level:
>>>>>>> theirs
        publish(board)
    return find(board, basin)
