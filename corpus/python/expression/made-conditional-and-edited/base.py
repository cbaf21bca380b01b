def caption(row):
    text = describe(row.height)
    return text
