def flows(board):
    ports = board.ports()
    flow = dict.fromkeys(board.edges(), 0.0)
    return flow
