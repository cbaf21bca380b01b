def start(station):
    station.unit = "m"
    run(station)
