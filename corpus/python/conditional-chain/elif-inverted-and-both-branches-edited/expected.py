def show(gauge):
    if gauge.wet:
<<<<<<< ours
        draw(gauge)
    elif not gauge.deep:
        send(gauge)
    else:
        log(gauge)
=======
        draw(gauge, 1)
    elif gauge.deep:
        log(gauge, "deep")
    else:
        send(gauge, "now")
>>>>>>> theirs
