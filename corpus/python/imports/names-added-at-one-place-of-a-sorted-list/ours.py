from tideboard.model import High, Low, Spring


def kinds():
    return [High, Low]
