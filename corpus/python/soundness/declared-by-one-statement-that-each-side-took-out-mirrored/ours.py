def chart(table, station):
    if station not in table:
        table[station] = tide
    else:
        tide = table[station]
    return draw(tide)


def report(stations):
    for station in stations:
        tide = measure(station)
        show(station)
