chart = board.plot(
    tides,
    grid=10,
<<<<<<< ours
    legend=2,
=======
    legend=1,
>>>>>>> theirs
    scale=1,
)
