def refresh(station):
    # The table of the day.
    station.check(page)
    store(station)
    return station
