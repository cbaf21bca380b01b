def run(station):
    start(station)
    with lock(station), session(station):
        rows = read()
        check(rows)
    stop(station)
