def settle(quay):
    quay.marks.append(value)
    with quay.lock(timeout=3):
        log("settled now", quay)
        quay.close()
    notify(quay)
    if quay.name in names:
        warn(quay)
        value = args[quay.place]
    elif quay.name in words:
        value = words[quay.name]
