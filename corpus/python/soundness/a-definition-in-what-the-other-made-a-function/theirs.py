log("start")
for station in range(3):
    levels = read(station)
    draw(levels, station)
try:
    chart = plot(1)
    save(chart)
except ValueError:
    log("no chart")


def tide(port):
    return port.level


log("drawn")
log("done")
log(tide(HARBOUR))
