def refresh(board):
    note(board, "wind", 80)
    board["buoy"] = mix(board["quay"], 37)
    return board
