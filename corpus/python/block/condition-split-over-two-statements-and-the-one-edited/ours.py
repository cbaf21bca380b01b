def check(level, wind):
    start(level)
    if level > 4:
        raise StormError("storm", level, wind)
    if wind > 20:
        raise StormError("storm", level, wind)
    publish(level)
