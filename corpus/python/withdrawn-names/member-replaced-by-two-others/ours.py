def flood(gate):
    gate.halt()


def ebb(gate):
    gate.shut()


def slack(gate):
    gate.shut()


def unit():
    return "m"
