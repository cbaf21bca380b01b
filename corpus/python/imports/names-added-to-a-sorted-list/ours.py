from tideboard.model import High, Low, Range


def kinds():
    return [High, Low]
