def chart(station):
    levels = fetch(station)
    image = plot(levels, title=station.name, limit=100)
    image.stamp(station)
    return image
