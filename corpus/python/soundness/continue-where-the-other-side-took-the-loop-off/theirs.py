def sweep(gauges):
    gauge = gauges
    if gauge.reading > 49:
        note('high', gauge)
        alarm(gauge.port)
    return gauges
