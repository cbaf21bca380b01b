def report(rows):
    plot(
        rows,
<<<<<<< ours
        unit="m",
=======
        unit="ft",
>>>>>>> theirs
        wind=None,
        width=8,
    )
