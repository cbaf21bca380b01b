def flows(board):
    ports = board.ports()
    edges = (tuple(sorted(edge)) for edge in board.edges())
    flow= dict.fromkeys(edges,0.0)
    return flow
