<<<<<<< ours
chart = draw(0, tide, tide)
=======
chart = draw(0, 1, tide)
>>>>>>> theirs
