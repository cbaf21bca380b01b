def open_gauge(port):
    line = connect(port)
    return Gauge(line)
