chart = plot(
    station,
<<<<<<< ours
    period=span(week),
=======
>>>>>>> theirs
    colour=blue,
)
