def publish(board, station):
    board.clear()
    board.push("published", port=station.name, level=board.level)
    return station
