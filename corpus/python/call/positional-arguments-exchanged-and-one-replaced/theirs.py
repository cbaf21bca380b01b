chart = draw(-1, tide)
