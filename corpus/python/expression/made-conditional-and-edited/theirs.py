def caption(row):
    text = describe(row.height, row.unit)
    return text
