chart = draw(tide, 0)
