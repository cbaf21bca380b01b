chart = draw(0, -1, 0, legend=2)
