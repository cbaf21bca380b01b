def names(stations):
    return join([s.name for s in stations])

X = {s.name for s in stations if s.open}
