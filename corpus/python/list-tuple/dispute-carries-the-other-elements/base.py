ports = ["dover", "wick"]
show(ports)
