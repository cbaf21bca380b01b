low = 1

<<<<<<< ours
Rows = Level[gauge.Row[Port], Port]
=======
Rows = Level[Either[Port, gauge.Row[Port]], Port]
>>>>>>> theirs
