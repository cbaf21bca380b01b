def flood(gate):
    gate.stop()


def ebb(gate):
    gate.stop()


def slack(gate):
    gate.stop()
    gate.log("slack")


def storm(gate):
    gate.lower()
    gate.stop()


def unit():
    return "m"
