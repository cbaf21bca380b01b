log(1, unit=2, berth=quay)
log(2)
