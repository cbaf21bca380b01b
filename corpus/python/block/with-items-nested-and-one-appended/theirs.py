def run(station):
    start(station)
    with lock(station), session(station), timer(station):
        rows = read()
        check(rows)
    stop(station)
