chart = board.plot(tides, scale=0)
