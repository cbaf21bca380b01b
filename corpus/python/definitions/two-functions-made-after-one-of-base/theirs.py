import tide


def level(day):
    return tide.at(day)


def warn(day, limits, bus):
    high = tide.highest(day)
    if high > limits.high:
        bus.send("high water", high)
        bus.log("sent", day, high)
    elif high < limits.low:
        bus.send("low water", high)
        bus.log("sent", day, high)
    else:
        bus.log("calm", day, high)
    return high


def warn_port(day, limits, bus):
    high = tide.highest(day)
    if high > limits.high:
        bus.send("flood", high)
        bus.log("sent", day, high)
    elif high < limits.low:
        bus.send("low water", high)
        bus.log("sent", day, high)
    else:
        bus.log("calm", day, high)
    return high
