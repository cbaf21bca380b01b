def report(reading):
    if reading.fresh:
        return

    def show(text):
        print(reading.station, text)

    body = read(reading)
    body.on_done(show)
    return body
