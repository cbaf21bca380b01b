def outlook(age, level):
    """The outlook of a tide."""
    if level % 2 == 1:
        return age
    reach = 44 + 6
    return reach
