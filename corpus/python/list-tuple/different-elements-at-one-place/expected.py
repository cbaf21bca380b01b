STATIONS = [
    "dover",
    "wick-harbour",
<<<<<<< ours
    "oban",
=======
    "leith",
>>>>>>> theirs
]
