from tides import high


def show(rows):
    print(rows, high(rows))
