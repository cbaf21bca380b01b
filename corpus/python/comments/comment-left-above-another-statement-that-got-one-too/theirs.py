def refresh(station):
    # Rows of the page.
    store(rows)
    if calm:
        return rows
