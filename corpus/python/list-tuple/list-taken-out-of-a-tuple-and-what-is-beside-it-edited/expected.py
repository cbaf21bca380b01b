def read(page):
    rows = [parse(page)]
<<<<<<< ours
    return [rows, page.title]
=======
    return ([rows, page.title], page.unit)
>>>>>>> theirs
