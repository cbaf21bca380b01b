def publish(board, rows):
    if board.legacy:
        board.push_old(rows)
        return
    board.push(rows)
