def report(rows):
    plot(
        rows,
        unit="ft",
        wind=None,
        width=8,
    )
