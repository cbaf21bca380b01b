def cut(residual, board):
    # Remove what is full from the residual board for computing
    # the smallest cut.
    full = [(u, v, d) for u, v, d in board.edges(data=True)
            if d["flow"] == d["capacity"]]
    residual.remove_from(full)

    return residual
