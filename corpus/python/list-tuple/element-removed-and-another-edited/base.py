columns = ("time", "height", "kind", "station")
