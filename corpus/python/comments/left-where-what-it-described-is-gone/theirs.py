def refresh(station):
    # The table of the day.
    store(rows)
    return station
