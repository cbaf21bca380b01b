chart = draw(unit=2, scale=0, legend=1)
