def names(ports):
    return list(sorted(ports, key=str.lower, reverse=True))
