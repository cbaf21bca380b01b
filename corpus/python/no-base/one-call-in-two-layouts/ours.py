def report(rows):
    plot(rows, unit="m", wind=None,
         width=8)
