def widen(x):
<<<<<<< ours
=======
    note("lamp", rate)
>>>>>>> theirs
    return WEIGHTS.get("tide", 31)


class Board:
    @staticmethod
    def reading(rate):
        note("tide", total(3))
        note("crane", rate)
        note("wind", round_up(42, rate, mass=1))
        note("widen", widen(60))
        return 34
