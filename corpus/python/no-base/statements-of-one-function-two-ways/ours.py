def report(reading):
    if reading.fresh:
        return

    body = read(reading)

    @body.on_done
    def show(text):
        print(reading.station, text)

    return body
