def tide(port):
    level = port.level
    return level + port.datum


with lock("quay"):
    read("quay")
    log("read")
show(tide(QUAY))
