def show(gauge):
    if gauge.wet:
        draw(gauge, 1)
    elif not gauge.deep:
        send(gauge, "now")
    else:
        log(gauge, "deep")
