def refresh(station):
    station.check(page)
    store(station)
    return station
