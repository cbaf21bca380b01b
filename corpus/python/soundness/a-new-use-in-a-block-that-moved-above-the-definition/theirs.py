with lock("quay"):
    read("quay")
    log("read")


def tide(port):
    level = port.level
    return level + port.datum


show(tide(QUAY))
