def refresh(board):
    if board["lamp"]:
        note(board, "gauge", 46)
    else:
        note(board, "tide", 16)
    for _ in range(2):
        board["wind"] += board["level"]
        board["buoy"] -= 78
    publish(board)
