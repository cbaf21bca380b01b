assert reading.time < chart.end
assert reading.port == chart.port
