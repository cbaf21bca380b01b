def report(reading):
    if reading.fresh:
        return

<<<<<<< ours
=======
    @body.on_done
>>>>>>> theirs
    def show(text):
        print(reading.station, text)

    body = read(reading)
<<<<<<< ours
    body.on_done(show)
=======
>>>>>>> theirs
    return body
