def cut(residual, board):
    # Remove what is full from the residual board
    residual.remove_from((u, v) for u, v, d in board.edges(data=True)
                         if d["flow"] == d["capacity"])

    return residual
