def f():
    unit("m")
    marks(
        "m",
        "ft",
