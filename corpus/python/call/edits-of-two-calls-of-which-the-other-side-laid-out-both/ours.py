def f():
    unit("m", "ft")
    marks(
        "m",
    )
