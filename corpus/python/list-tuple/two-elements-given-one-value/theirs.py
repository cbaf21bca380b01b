UNITS = ["metres", "centimetres", "fathoms"]
