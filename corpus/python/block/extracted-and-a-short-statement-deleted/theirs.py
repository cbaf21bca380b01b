def refresh(board):
    board.clear()
    for gauge in board.gauges:
        refresh_one(board, gauge)
    return board


def refresh_one(board, gauge):
    gauge.wake()
    level = gauge.read(retries=3, timeout=board.timeout)
    board.show(gauge, level)
