def refresh(station):
    # The table of the day.
    rows = parse(station.page)
    store(rows)
    return station
