ports = ["deal", "wick", "leith"]
show(ports)
