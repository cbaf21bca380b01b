chart = draw(1, 0, 0, legend=2)
