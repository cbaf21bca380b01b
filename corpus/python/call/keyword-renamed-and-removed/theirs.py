chart = plot(
    station,
    colour=blue,
)
