def refresh(station):
    # Rows of the page.
    # Mind the gauge.
    store(rows, unit="ft")
    if calm:
        return rows
