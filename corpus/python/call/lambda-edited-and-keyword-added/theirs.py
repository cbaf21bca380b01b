def ranking(rows):
    return sorted(rows, key=lambda row: (row.day, row.time))
