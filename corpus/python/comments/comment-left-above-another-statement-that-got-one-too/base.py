def refresh(station):
    # Rows of the page.
    rows = parse(
        page)
    store(rows)
    return rows
