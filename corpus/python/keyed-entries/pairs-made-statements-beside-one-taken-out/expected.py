def measure(span):
    row = {}
    row['tide'] = span
<<<<<<< ours
    row['unit'] = 'm'
=======
>>>>>>> theirs
    row['by'] = 1
    note(row)
