def forecast(station):
    if station.is_open(wide=True):
        if station.lamp:
            settings = {
                'unit': 'm',
            }
            settings['wide'] = True
            settings = {
                'zone': 'UTC',
            }
        station.note('tide', forecast(station.next), forecast(station.last))
    return sum(station.depths)
