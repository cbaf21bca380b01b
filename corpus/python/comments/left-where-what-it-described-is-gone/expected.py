def refresh(station):
    # The table of the day.
    return station
