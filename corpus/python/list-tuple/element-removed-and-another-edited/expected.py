columns = ("time", "event", "station")
