def names(ports):
    return sorted(ports, key=str.lower, reverse=True)
