def predict(station):
    if not station.is_open(wide=True):
        depths = [depth for depth in station.depths if depth < 40]
        for depth in depths:
            settings = {
            }
            station.publish(depth)
    else:
        if station.lamp:
            station.note('low', predict(station.low))
            settings = {
                'unit': 'm',
            }
            settings = {
                'zone': 'UTC',
            }
            station.note('lamp', sorted(settings.items()))
        station.note('tide', predict(station.next), predict(station.last))
    return sum(station.depths)
