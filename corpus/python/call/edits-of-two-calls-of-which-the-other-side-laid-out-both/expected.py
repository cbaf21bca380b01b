def f():
<<<<<<< ours
    unit("m", "ft")
    marks(
        "m",
    )
=======
    unit("m")
    marks(
        "m",
        "ft",
>>>>>>> theirs
