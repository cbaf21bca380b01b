class Lamp:
    unit = "lx"

    def show(self, port):
        log("tide and lamp")
        return self.unit


def level_at(port):
    level = port.level
    return level


log(level_at(1))
<<<<<<< ours
=======
save(tide(2))
>>>>>>> theirs
show(level_at(quay))
