def show(gauge):
    if gauge.wet:
        draw(gauge)
    elif not gauge.deep:
        send(gauge)
    else:
        log(gauge)
