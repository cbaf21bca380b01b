log(1, unit=2, berth=quay, datum=3)
log(2)
level = 3
