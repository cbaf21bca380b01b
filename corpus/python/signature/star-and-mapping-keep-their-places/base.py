def draw(series, *, width=640, **style):
    canvas = Canvas(width)
    canvas.plot(series, **style)
