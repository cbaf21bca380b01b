chart = draw(0, -1, tide, legend=2)
