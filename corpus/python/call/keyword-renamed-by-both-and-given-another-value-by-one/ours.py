plot(levels, ticks=2)
