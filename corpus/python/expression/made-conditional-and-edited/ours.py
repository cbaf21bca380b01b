def caption(row):
    text = describe(row.height) if row else "no data"
    return text
