rows = parse(page)
store(rows)
