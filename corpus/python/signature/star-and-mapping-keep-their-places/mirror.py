def draw(series, title, *, width=640, legend=False, height=320, **style):
    canvas = Canvas(width)
    canvas.plot(series, **style)
