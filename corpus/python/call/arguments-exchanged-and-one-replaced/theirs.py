record(level, port)
