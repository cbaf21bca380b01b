def caption(row):
    text = describe(row.height, row.unit) if row else "no data"
    return text
