import board


@board.page
def tides():
    return board.draw("tides")


@board.page
def storms():
    return board.draw("storms")
