plot(levels, dpi=2)
