chart = draw(dpi=2, unit=2, legend=1)
