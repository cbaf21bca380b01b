<<<<<<< ours
chart = board.plot(tides, scale=10, width=2)
=======
chart = board.plot(tides, scale=10, width=0)
>>>>>>> theirs
