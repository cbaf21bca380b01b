plot(station,
     tides, width=8,
     'levels of '
     'the whole day')
