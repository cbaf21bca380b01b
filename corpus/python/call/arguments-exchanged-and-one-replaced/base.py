record(level, harbour)
