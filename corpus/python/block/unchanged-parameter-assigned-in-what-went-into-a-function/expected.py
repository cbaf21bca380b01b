def outlook(age, level):
    """The outlook of a tide."""
    def inner():
        if level % 2 == 1:
            return age
<<<<<<< ours
        reach = 44 + 6
=======
        level = 44 + 6
>>>>>>> theirs
        return reach
    return inner()
