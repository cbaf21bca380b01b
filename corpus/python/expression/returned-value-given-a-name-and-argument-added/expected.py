def chart(station):
    levels = fetch(station)
    image = plot(levels, title=station.name, limit=100, unit="ft")
    image.stamp(station)
    return image
