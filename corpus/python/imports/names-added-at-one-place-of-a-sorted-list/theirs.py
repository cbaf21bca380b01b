from tideboard.model import High, Low, Neap


def kinds():
    return [High, Low]
