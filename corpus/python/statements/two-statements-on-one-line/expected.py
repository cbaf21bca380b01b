def origin(chart):
    x = chart.left + 4; y = chart.bottom
    return x, y
