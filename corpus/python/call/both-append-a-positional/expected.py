def crest(first, second):
<<<<<<< ours
    height = max(first, second, third())
=======
    height = max(first, second, surge())
>>>>>>> theirs
    return round(height, 1)
