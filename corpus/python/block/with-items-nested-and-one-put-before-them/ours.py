def run(station):
    with lock(station):
        s.prepare()
        with session(station) as s:
            s.read()
            s.write()
