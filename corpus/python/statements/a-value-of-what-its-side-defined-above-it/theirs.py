UNIT = "m"
SCALE = 2
