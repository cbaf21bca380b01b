columns = ("time", "height", "event", "station")
