chart = plot(station, period=span(week))
