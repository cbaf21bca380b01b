def colour(level):
    if level > 5:
        return "red"
    else:
        return "green"
