def refresh(board, port, season):
    board.lock()
    for gauge in board.gauges:
        reading = gauge.read(port)
        board.show(gauge, reading)
        board.log('shown', gauge, port)
    board.unlock()
