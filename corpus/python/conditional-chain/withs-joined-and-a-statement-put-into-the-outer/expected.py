def a():
<<<<<<< ours
    with open(x) as f, open(y) as g:
        copy(f, g)
=======
    with open(x) as f:
        check(f)
        with open(y) as g:
            copy(f, g)
>>>>>>> theirs
