from tideboard.wire import u


def greeting(station):
<<<<<<< ours
    station.write(b("ebb"), b"tide ")
    station.write(b("end"))
=======
    station.write(b"ebb", b"tide ")
    station.write(b"end")
>>>>>>> theirs
    station.close()
