def check(level, wind):
    start(level)
    if level > 4 or wind > 20:
        raise StormError("storm", level, wind)
    publish(level)
