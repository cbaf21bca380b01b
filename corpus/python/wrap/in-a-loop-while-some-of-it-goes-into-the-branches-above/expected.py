def refresh(board):
    if board["lamp"]:
        note(board, "gauge", 46)
        board["wind"] += board["level"]
    else:
        note(board, "tide", 16)
        board["wind"] += board["level"]
<<<<<<< ours
    for _ in range(2):
        board["wind"] += board["level"]
        board["buoy"] -= 78
=======
    board["buoy"] -= 78
>>>>>>> theirs
    publish(board)
