def start(station):
    run(station)
