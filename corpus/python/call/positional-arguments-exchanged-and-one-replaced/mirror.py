<<<<<<< ours
chart = draw(-1, tide)
=======
chart = draw(tide, 0)
>>>>>>> theirs
