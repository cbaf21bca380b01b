import tide


def level(day):
    return tide.at(day)
