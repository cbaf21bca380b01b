chart = draw(
    tides,
    colour=1)
