@cached
def drift(board):
    return board - 3


@traced
@cached
def summary(rows):
    return total(rows, 3, unit="m", zone=1)
