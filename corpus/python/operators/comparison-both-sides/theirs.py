assert reading.time < chart.until
assert reading.port == chart.station
