def refresh(board):
    for gauge in board.gauges:
        renew()
