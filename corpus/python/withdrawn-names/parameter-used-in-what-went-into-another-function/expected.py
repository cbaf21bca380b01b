def refresh(board, port, season):
    board.lock()
    show_all(board, port)
    board.unlock()


def show_all(board, port):
    for gauge in board.gauges:
        reading = gauge.read(port)
        board.show(gauge, reading)
<<<<<<< ours
        board.log('shown', gauge, port)
=======
        board.log('shown', gauge, port, season)
>>>>>>> theirs
