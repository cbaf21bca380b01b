def draw(series, *, width=640, height=320, **style):
    canvas = Canvas(width)
    canvas.plot(series, **style)
