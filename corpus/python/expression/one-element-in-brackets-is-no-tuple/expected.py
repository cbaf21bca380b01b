def args(level):
<<<<<<< ours
    names = (level,)
=======
    names = level
>>>>>>> theirs
    return draw(level)
