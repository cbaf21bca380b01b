<<<<<<< ours
plot(levels, ticks=1)
=======
plot(levels, ticks=2)
>>>>>>> theirs
