<<<<<<< ours
chart = board.plot(tides, scale=10, width=0)
=======
chart = board.plot(tides, scale=10, width=2)
>>>>>>> theirs
