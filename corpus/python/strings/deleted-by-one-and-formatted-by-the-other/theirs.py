def show(level):
    raise TideError(
        "no level of "
        "%r today" % level
    )


def low(day):
    return "low"
