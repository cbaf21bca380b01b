UNITS = ["centimetres", "feet", "fathoms"]
