def origin(chart):
    x = chart.left; y = chart.top
    return x, y
