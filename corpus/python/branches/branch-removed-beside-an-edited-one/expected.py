def colour(level):
    if level > 5:
        return "crimson"
    else:
        return "teal"
