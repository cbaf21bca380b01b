def refresh(board):
    board.clear()
    for gauge in board.gauges:
        gauge.wake()
        level = gauge.read(retries=5, timeout=board.timeout)
        board.show(gauge, level)
    return board
