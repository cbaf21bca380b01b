def sweep(gauges):
<<<<<<< ours
    for gauge in gauges:
        if gauge.reading <= 49:
            continue
=======
    gauge = gauges
    if gauge.reading > 49:
>>>>>>> theirs
        note('high', gauge)
        alarm(gauge.port)
    return gauges
