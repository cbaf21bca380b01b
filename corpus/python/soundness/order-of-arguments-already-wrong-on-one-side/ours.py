plot(station,
     tides, width=8,
     'levels of '
     'the day')
