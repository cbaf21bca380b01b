<<<<<<< ours
ports = ["deal", "wick", "oban"]
=======
ports = ["deal", "wick", "leith"]
>>>>>>> theirs
show(ports)
