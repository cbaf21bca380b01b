figure = plot(series, smooth=5, color="teal", grid=True)
figure.save("today.png")
