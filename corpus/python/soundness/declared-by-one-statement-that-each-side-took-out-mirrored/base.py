def chart(table, station):
    if station not in table:
        tide = measure(station)
        table[station] = tide
    else:
        tide = table[station]
    return draw(tide)


def report(stations):
    for station in stations:
        show(station)
