def plan(cargo, draught):
<<<<<<< ours
    if not (cargo <= 40 or draught <= 3):
=======
    if not (cargo > 40 and draught > 3):
>>>>>>> theirs
        return hold(cargo)
    return berth(cargo)
