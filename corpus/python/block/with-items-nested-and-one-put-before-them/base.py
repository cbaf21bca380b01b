def run(station):
    with lock(station), session(station) as s:
        s.read()
        s.write()
