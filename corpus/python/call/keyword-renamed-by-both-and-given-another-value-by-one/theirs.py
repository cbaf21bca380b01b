plot(levels, ticks=1)
