def publish(board, rows):
    board.push(rows, atomic=True)
    board.stamp()
