class Lamp:
    unit = "lx"
    step = 7

    def show(self, port):
        log("tide and lamp")
        return self.unit


def level_at(port):
    level = port.level
    return level


log(level_at(1))
show(level_at(quay))
