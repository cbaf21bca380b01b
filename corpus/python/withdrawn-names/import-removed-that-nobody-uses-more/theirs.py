import json
from tides import high, low


def show(rows):
    print(json.dumps(rows), high(rows))
    print(low(rows))
