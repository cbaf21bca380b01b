def run(station):
    start(station)
    with lock(station):
        begin(station)
        with session(station):
            rows = read()
            check(rows)
    stop(station)
