chart = draw(0, 1, tide)
