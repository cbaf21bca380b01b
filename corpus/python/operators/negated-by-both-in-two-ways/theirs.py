def plan(cargo, draught):
    if not (cargo > 40 and draught > 3):
        return hold(cargo)
    return berth(cargo)
