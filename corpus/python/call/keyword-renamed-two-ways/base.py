chart = plot(station, days=span(week))
