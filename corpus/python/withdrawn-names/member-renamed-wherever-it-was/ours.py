def flood(gate):
    gate.halt()


def ebb(gate):
    gate.halt()


def slack(gate):
    gate.halt()


def unit():
    return "m"
