def a():
<<<<<<< ours
    level -= 2
=======
    level += 3
>>>>>>> theirs
