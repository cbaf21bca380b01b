<<<<<<< ours
chart = plot(station, range=span(week))
=======
chart = plot(station, period=span(week))
>>>>>>> theirs
