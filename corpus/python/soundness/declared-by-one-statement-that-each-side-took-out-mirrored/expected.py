def chart(table, station):
    if station not in table:
<<<<<<< ours
        table[station] = tide
=======
        tide = measure(station)
        table[station.name] = tide
>>>>>>> theirs
    else:
        known = table[station]
    return draw(tide)


def report(stations):
    for station in stations:
        tide = measure(station)
        show(station)
