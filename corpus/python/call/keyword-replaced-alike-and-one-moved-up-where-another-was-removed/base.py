chart = draw(
    tides,
    legend=0,
    grid=1)
