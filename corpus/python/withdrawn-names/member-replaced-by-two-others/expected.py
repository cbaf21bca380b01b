def flood(gate):
    gate.halt()


def ebb(gate):
    gate.shut()


def slack(gate):
    gate.shut()
    gate.log("slack")


def storm(gate):
    gate.lower()
    gate.stop()


def unit():
    return "m"
