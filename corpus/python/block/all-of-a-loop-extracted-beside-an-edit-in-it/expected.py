def refresh(board):
    board.clear()
    for gauge in board.gauges:
        gauge.renew()
    return board


def renew(gauge, board):
    gauge.wake()
    level = gauge.read(retries=5, timeout=board.timeout)
    board.show(gauge, level)
