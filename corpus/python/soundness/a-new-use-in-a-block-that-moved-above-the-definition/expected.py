with lock("quay"):
    read("quay")
    log("read")


def tide(port):
    level = port.level
    return level + port.datum


<<<<<<< ours
with lock("quay"):
    log(tide(HARBOUR))
    read("quay")
    log("read")
=======
>>>>>>> theirs
show(tide(QUAY))
