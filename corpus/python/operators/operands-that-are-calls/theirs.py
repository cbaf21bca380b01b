def total(port):
    return astronomic(port, days=7) + surge(port, days=7, model="east")
