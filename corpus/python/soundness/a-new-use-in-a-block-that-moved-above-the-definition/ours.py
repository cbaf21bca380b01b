def tide(port):
    level = port.level
    return level + port.datum


with lock("quay"):
    log(tide(HARBOUR))
    read("quay")
    log("read")
show(tide(QUAY))
