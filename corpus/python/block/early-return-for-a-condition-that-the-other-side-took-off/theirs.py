def publish(board, port):
    rows = board.rows(port)
    note('mark', port, scale=54)
    return rows
