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
            settings['wide'] = True
            settings = {
                'zone': 'UTC',
            }
<<<<<<< ours
            station.note('lamp', sorted(settings.items()))
        station.note('tide', predict(station.next), predict(station.last))
=======
        station.note('tide', forecast(station.next), forecast(station.last))
>>>>>>> theirs
    return sum(station.depths)
