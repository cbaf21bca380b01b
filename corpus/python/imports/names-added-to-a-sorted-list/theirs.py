from tideboard.model import Datum, High, Low


def kinds():
    return [High, Low]
