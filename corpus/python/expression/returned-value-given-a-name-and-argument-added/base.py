def chart(station):
    levels = fetch(station)
    return plot(levels, title=station.name, limit=100)
