plot(station,
     tides,
     'levels of '
     'the day')
