def flood(gate):
    gate.stop()


def ebb(gate):
    gate.stop()


def slack(gate):
    gate.stop()


def unit():
    return "m"
