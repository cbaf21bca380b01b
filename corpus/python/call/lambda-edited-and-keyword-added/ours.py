def ranking(rows):
    return sorted(rows, key=lambda row: row.time, reverse=True)
