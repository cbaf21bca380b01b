def publish(board, rows):
    if board.legacy:
        board.push_old(rows, retry=True)
        return None
    board.push(rows, atomic=True)
