import tide


def level(day):
    return tide.at(day)


def warn_port(day, limits, bus):
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
