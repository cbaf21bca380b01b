figure = plot(series, color="teal")
figure.save("today.png")
