# Heights are in metres.

def height(gauge):
    return gauge.read() + gauge.datum


def name(gauge):
    return gauge.label.strip()


def station(gauge):
    return gauge.station or "unknown"
