def run(station):
    start(station)
<<<<<<< ours
    with lock(station):
        begin(station)
        with session(station):
            rows = read()
            check(rows)
=======
    with lock(station), session(station), timer(station):
        rows = read()
        check(rows)
>>>>>>> theirs
    stop(station)
