chart = plot(station, range=span(week))
