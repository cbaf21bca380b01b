chart = draw(tide, -1)
