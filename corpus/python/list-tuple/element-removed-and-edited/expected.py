<<<<<<< ours
columns = ("time", "port")
=======
columns = ("time", "level", "port")
>>>>>>> theirs
