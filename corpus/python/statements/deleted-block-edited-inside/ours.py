def publish(board, rows):
    board.push(rows)
