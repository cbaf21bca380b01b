from tides import high, low


def show(rows):
    print(rows, high(rows))
    print(low(rows))
