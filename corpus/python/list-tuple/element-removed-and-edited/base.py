columns = ("time", "height", "station")
