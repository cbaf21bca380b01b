<<<<<<< ours
chart = draw(0, 1, tide)
=======
chart = draw(0, tide, tide)
>>>>>>> theirs
