plot(station,
     tides,
     'levels of '
     'the whole day')
