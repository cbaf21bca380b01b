def refresh(board):
    for gauge in board.open_gauges():
        renew()
