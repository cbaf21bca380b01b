def refresh(board):
    note(board, "wind", 80)
    step(board)
    return board


def step(board):
    board["buoy"] = mix(board["quay"], 37)
    board["buoy"] -= 94
    return board
