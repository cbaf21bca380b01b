chart = draw(
    tides,
    legend=0,
    colour=1)
