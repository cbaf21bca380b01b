def colour(level):
    if level > 5:
        return "red"
    elif level > 4:
        return "orange"
    elif level < 0:
        return "blue"
    else:
        return "lime"
