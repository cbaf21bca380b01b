from tideboard.model import High, Low


def kinds():
    return [High, Low]
