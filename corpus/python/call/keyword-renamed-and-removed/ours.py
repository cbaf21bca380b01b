chart = plot(
    station,
    period=span(week),
    colour=blue,
)
