record(harbour, level)
