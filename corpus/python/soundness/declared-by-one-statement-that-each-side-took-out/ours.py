def chart(table, station):
    if station not in table:
        tide = measure(station)
        table[station.name] = tide
    else:
        known = table[station]
    return draw(tide)


def report(stations):
    for station in stations:
        show(station)
