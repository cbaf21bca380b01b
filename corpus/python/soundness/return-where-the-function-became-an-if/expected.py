from tideboard import gauge


<<<<<<< ours
if gauge.ready:
=======
def refresh():
>>>>>>> theirs
    level = gauge.read()
    store(level)

    chart = draw(level)
    publish(chart)

<<<<<<< ours
=======
    if not chart:
        return
>>>>>>> theirs
    log("refreshed")
