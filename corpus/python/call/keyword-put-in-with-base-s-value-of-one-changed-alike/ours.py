chart = board.plot(tides, scale=10, width=2)
