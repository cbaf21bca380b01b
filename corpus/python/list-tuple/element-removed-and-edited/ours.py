columns = ("time", "station")
