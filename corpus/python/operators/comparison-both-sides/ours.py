assert reading.stamp < chart.end
assert reading.port == chart.port
