figure = plot(series, smooth=3, color="teal")
figure.save("today.png")
