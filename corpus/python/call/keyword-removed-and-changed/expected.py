<<<<<<< ours
figure = plot(series, color="teal", grid=True)
=======
figure = plot(series, smooth=5, color="teal", grid=True)
>>>>>>> theirs
figure.save("today.png")
