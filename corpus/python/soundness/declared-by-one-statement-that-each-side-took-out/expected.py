def chart(table, station):
    if station not in table:
<<<<<<< ours
        tide = measure(station)
        table[station.name] = tide
=======
        table[station] = tide
>>>>>>> theirs
    else:
        known = table[station]
    return draw(tide)


def report(stations):
    for station in stations:
        tide = measure(station)
        show(station)
