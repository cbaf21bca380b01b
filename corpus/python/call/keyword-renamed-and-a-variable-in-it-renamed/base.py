def publish(board, station):
    board.clear()
    board.push("published", port=station, level=board.level)
    return station
