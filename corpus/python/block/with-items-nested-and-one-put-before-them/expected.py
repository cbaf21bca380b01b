def run(station):
    with timer(), lock(station):
        s.prepare()
        with session(station) as s:
            s.read()
            s.write()
