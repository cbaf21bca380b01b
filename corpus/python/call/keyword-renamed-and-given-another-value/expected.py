def publish(board, station):
    board.clear()
<<<<<<< ours
    board.push("published", harbour=station, level=board.level)
=======
    board.push("published", port=station.name, level=board.level)
>>>>>>> theirs
    return station
