chart = board.plot(
    tides,
    grid=1,
    scale=1,
)
