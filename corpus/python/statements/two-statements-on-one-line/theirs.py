def origin(chart):
    x = chart.left; y = chart.bottom
    return x, y
