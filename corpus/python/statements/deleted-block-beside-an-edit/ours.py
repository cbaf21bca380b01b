def publish(board, rows):
    board.push(rows)
    board.stamp()
