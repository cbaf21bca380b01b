def refresh(station):
    # Rows of the page.
    rows = parse(
        page)
    # Mind the gauge.
    store(rows, unit="ft")
    return rows
