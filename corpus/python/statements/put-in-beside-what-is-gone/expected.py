def open_gauge(port):
    line = connect(port)
<<<<<<< ours
=======
    line.set_blocking(False)
    line.set_retries(3)
>>>>>>> theirs
    return Gauge(line)
