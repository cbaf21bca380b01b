rows = parse(page, strict=True)
store(rows)
