def colour(level):
    if level > 5:
        return "red"
    elif level > 4:
        return "amber"
    elif level < 0:
        return "blue"
    else:
        return "lime"
