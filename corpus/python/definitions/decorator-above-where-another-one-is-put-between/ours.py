@cached
def drift(board):
    return board - 3


@cached
def summary(rows):
    return total(rows, 3, unit="m")
