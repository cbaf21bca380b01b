def refresh(board):
    for gauge in board.open_gauges():
        gauge.wake()
        level = gauge.read(retries=3)
        board.show(gauge, level)
