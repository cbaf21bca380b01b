columns = ("time", "kind", "station")
