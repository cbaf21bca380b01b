chart = draw(0, tide, tide)
