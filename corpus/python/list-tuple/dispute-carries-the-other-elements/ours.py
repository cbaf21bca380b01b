ports = ["dover", "wick", "oban"]
show(ports)
