def publish(board, gauge):
    board.clear()
    board.push("published", harbour=gauge, level=board.level)
    return gauge
