def colour(level):
    if level > 5:
        return "red"
    elif level > 4.5:
        return "amber"
    elif level >= 4:
        return "orange"
    else:
        return "green"
