def run(board, tide):
    exec tide.code % board.name in board.scope
    return show(
        board,
    )
