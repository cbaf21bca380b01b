from tideboard.model import Datum, High, Low, Range


def kinds():
    return [High, Low]
