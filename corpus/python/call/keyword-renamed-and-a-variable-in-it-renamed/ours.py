def publish(board, station):
    board.clear()
    board.push("published", harbour=station, level=board.level)
    return station
