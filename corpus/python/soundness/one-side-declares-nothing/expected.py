log(1, unit=2, datum=3, berth=quay)
log(2)
level = 3
