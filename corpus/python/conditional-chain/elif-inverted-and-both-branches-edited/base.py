def show(gauge):
    if gauge.wet:
        draw(gauge)
    elif gauge.deep:
        log(gauge)
    else:
        send(gauge)
