def settle(quay):
    if quay.name in names:
        check(quay)
        value = args[quay.place]
    elif quay.name in words:
        value = words[quay.name]
    with quay.lock(timeout=3):
        log("settled")
        quay.close()
    quay.marks.append(value)
    notify(quay)
