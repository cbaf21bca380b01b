record(port, level)
