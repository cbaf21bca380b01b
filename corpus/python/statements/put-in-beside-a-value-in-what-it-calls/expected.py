def start(station):
<<<<<<< ours
=======
    station.unit = "m"
    station.reload()
>>>>>>> theirs
    run(station)
