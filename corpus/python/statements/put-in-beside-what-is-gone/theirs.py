def open_gauge(port):
    line = connect(port)
    line.set_blocking(False)
    line.set_retries(3)
    return Gauge(line)
