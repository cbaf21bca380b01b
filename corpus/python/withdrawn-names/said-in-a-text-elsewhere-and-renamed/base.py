class Lamp:
    unit = "lx"
    step = 7

    def show(self, port):
        log("tide and lamp")
        return self.unit


def tide(port):
    level = port.level
    return level


log(tide(1))
show(tide(quay))
