def publish(board, port):
    rows = board.rows(port)
<<<<<<< ours
    if not (port in board.gauges):
        return rows
=======
>>>>>>> theirs
    note('mark', port, scale=54)
    return rows
