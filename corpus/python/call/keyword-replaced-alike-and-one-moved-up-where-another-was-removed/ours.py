chart = draw(
    tides,
    grid=1,
    colour=1)
