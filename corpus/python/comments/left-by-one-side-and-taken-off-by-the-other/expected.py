def refresh(station):
    store(station)
    return station
