import json
from tides import high


def show(rows):
    print(json.dumps(rows), high(rows))
