def report(reading):
    if reading.fresh:
        return

    body = read(reading)

<<<<<<< ours
    @body.on_done
    def show(text):
        print(reading.station, text)

=======
    def show(text):
        print(reading.station, text)
    body.on_done(show)
>>>>>>> theirs
    return body
