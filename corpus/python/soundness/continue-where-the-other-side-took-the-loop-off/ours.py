def sweep(gauges):
    for gauge in gauges:
        if gauge.reading <= 49:
            continue
        note('high', gauge)
        alarm(gauge.port)
    return gauges
