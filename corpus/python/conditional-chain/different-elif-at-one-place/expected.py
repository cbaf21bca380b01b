def colour(level):
    if level > 5:
        return "crimson"
<<<<<<< ours
    elif level > 4:
        return "orange"
=======
    elif level > 3:
        return "yellow"
>>>>>>> theirs
    else:
        return "green"
