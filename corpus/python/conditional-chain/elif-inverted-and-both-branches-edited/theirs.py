def show(gauge):
    if gauge.wet:
        draw(gauge, 1)
    elif gauge.deep:
        log(gauge, "deep")
    else:
        send(gauge, "now")
