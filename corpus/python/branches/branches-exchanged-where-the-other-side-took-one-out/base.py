def forecast(station):
    if station.is_open(wide=True):
        if station.lamp:
            settings = {
                'unit': 'm',
            }
            settings = {
                'zone': 'UTC',
            }
            station.note('lamp', sorted(settings.items()))
        station.note('tide', forecast(station.next), forecast(station.last))
    else:
        depths = [depth for depth in station.depths if depth < 40]
        for depth in depths:
            settings = {
            }
            station.publish(depth)
    return sum(station.depths)
