chart = board.plot(
    tides,
    grid=10,
    legend=2,
    scale=1,
)
