def refresh(board):
    for gauge in board.gauges:
        gauge.wake()
        level = gauge.read(retries=3)
        board.show(gauge, level)
