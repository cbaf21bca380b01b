def publish(board, rows):
    if board.legacy:
        for row in rows:
            board.push_old(row)
        return
    board.push(rows, atomic=True)
    board.stamp()
