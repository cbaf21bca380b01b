chart = {
    'scale': 0,
<<<<<<< ours
    'unit': 1,
=======
>>>>>>> theirs
    'grid': 10,
}
