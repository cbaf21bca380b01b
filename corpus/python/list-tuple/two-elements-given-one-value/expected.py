<<<<<<< ours
UNITS = ["centimetres", "feet", "fathoms"]
=======
UNITS = ["metres", "centimetres", "fathoms"]
>>>>>>> theirs
