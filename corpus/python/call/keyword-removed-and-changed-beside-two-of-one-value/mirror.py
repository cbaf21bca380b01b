<<<<<<< ours
chart = draw(dpi=2, scale=2, unit=2, legend=1)
=======
chart = draw(dpi=2, unit=2, legend=1)
>>>>>>> theirs
