def name(gauge):
    return gauge.label.strip()


def station(gauge):
    return gauge.station or "unknown"
