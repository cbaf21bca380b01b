def draw(series, title, *, width=640, height=320, legend=False, **style):
    canvas = Canvas(width)
    canvas.plot(series, **style)
