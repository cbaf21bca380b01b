def measure(wind):
    if wind > 3:
        row = total(wind)
    else:
        row = level(wind)
<<<<<<< ours
    note('row', sorted(row.items()))
=======
        note('rows', sorted(row.items()))
>>>>>>> theirs
    close(wind)
