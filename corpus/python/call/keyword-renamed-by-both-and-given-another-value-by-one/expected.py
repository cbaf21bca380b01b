<<<<<<< ours
plot(levels, ticks=2)
=======
plot(levels, ticks=1)
>>>>>>> theirs
