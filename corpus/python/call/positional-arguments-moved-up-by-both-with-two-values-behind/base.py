chart = draw(-1, 0, tide)
