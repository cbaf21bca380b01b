log(1, unit=2)
log(2)
