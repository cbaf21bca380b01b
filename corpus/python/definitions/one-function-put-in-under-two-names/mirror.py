import tide


def level(day):
    return tide.at(day)


<<<<<<< ours
def warn_port(day, limits, bus):
=======
def warn_harbour(day, limits, bus):
>>>>>>> theirs
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
