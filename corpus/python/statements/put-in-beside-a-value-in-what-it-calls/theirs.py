def start(station):
    station.unit = "m"
    station.reload()
    run(station)
