from tideboard.model import High, Low, Neap, Spring


def kinds():
    return [High, Low]
