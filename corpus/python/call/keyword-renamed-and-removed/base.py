chart = plot(
    station,
    days=span(week),
    colour=blue,
)
