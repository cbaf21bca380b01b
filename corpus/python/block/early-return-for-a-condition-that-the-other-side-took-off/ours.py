def publish(board, port):
    rows = board.rows(port)
    if not (port in board.gauges):
        return rows
    note('mark', port, scale=54)
    return rows
