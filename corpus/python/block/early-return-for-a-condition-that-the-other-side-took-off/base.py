def publish(board, port):
    rows = board.rows(port)
    if port in board.gauges:  # The authority reads this.
        note('mark', port, scale=54)
    return rows
