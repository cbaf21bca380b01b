def refresh(station):
    # The table of the day.
    store(station)
    return station
