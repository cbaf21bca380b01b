columns = ("time", "level", "port")
