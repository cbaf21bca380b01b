chart = board.plot(
    tides,
    grid=10,
    legend=1,
    scale=1,
)
