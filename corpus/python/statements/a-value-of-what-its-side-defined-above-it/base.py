UNIT = "m"
