class Board:
    @staticmethod
    def reading(rate):
        note("tide", total(3))
        note("crane", rate)
        note("wind", round_up(42, rate, mass=1))

        def widen(x):
            note("lamp", rate)
            return WEIGHTS.get("tide", 31)

        note("widen", widen(60))
        return 34
