UNIT = "m"
SCALE = 2


class Quay:
    lamps = 2


PORTS = [Quay]
