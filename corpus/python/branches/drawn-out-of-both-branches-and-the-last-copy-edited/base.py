def measure(wind):
    if wind > 3:
        row = total(wind)
        note('row', sorted(row.items()))
    else:
        row = level(wind)
        note('row', sorted(row.items()))
    close(wind)
