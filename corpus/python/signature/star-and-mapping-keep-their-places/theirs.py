def draw(series, title, *, width=640, legend=False, **style):
    canvas = Canvas(width)
    canvas.plot(series, **style)
