def run(station):
    with timer(), lock(station), session(station) as s:
        s.read()
        s.write()
