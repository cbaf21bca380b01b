<<<<<<< ours
chart = draw(tide, 0)
=======
chart = draw(-1, tide)
>>>>>>> theirs
