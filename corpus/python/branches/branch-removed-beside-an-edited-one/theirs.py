def colour(level):
    if level > 5:
        return "crimson"
    elif level > 4:
        return "orange"
    else:
        return "teal"
