from tideboard.wire import b, u


def greeting(station):
    station.write(b"ebb", b("tide "))
    station.write(b"end")
    station.close()
