def flood(gate):
    gate.halt()


def ebb(gate):
    gate.halt()


def slack(gate):
    gate.halt()
    gate.log("slack")


<<<<<<< ours
=======
def storm(gate):
    gate.lower()
    gate.stop()


>>>>>>> theirs
def unit():
    return "m"
