import board


# The first page that a visitor sees.
@board.page
def quays():
    return board.draw("quays", key="harbour")


@board.page
def tides():
    return board.draw("tides")


@board.page
def storms():
    return board.draw("storms")
