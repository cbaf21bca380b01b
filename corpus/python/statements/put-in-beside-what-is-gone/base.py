def open_gauge(port):
    line = connect(port)
    line.set_blocking(False)
    return Gauge(line)
