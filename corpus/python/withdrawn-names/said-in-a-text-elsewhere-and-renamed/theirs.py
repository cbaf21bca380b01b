class Lamp:
    unit = "lx"

    def show(self, port):
        log("tide and lamp")
        return self.unit


def tide(port):
    level = port.level
    return level


log(tide(1))
save(tide(2))
show(tide(quay))
