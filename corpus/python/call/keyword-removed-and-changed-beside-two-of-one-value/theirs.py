chart = draw(scale=2, unit=2, legend=1)
