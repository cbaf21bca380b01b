def settle(board):
    basin = draw(44)
<<<<<<< ours
    if basin and level:
=======
    if basin:
>>>>>>> theirs
        publish(board)
    return find(board, basin)
