def measure(span):
    row = {}
    row['tide'] = span
    row['unit'] = 'm'
    row['by'] = 1
    note(row)
