<<<<<<< ours
assert reading.stamp < chart.end
=======
assert reading.time < chart.until
>>>>>>> theirs
assert reading.port == chart.station
