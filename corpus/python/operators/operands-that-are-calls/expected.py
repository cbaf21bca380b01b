def total(port):
    return astronomic(port, days=14) + surge(port, days=7, model="east")
