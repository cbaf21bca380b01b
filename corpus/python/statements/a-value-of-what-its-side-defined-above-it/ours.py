UNIT = "m"


class Quay:
    lamps = 2


PORTS = [Quay]
