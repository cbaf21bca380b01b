def run(board, tide):
    exec tide.source % board.name in board.scope
    return show(
        board,
        unit="m",
    )
