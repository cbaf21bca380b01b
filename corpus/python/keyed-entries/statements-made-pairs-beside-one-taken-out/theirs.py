def measure(span):
    row = {}
    row['tide'] = span
    row['by'] = 1
    note(row)
