UNITS = ["metres", "feet", "fathoms"]
