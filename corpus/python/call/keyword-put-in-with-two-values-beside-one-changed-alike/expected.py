chart = board.plot(
    tides,
    grid=10,
<<<<<<< ours
    legend=1,
=======
    legend=2,
>>>>>>> theirs
    scale=1,
)
