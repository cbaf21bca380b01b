def draw(chart, level, wind):
    chart.plot(
        "tide",
        level,
        colour="blue",
        width=chart.width(1, wind),
    )
<<<<<<< ours
    chart.plot(
        "tide",
        -level,
        colour="grey",
        width=chart.width(1),
    )
=======
>>>>>>> theirs
