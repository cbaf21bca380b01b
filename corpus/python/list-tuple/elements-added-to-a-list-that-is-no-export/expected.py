rows = ["board"]
<<<<<<< ours
rows += ["gauge", "level", "port"]
=======
rows += ["gauge", "level", "chart"]
>>>>>>> theirs
