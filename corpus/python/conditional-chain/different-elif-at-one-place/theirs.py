def colour(level):
    if level > 5:
        return "crimson"
    elif level > 3:
        return "yellow"
    else:
        return "green"
