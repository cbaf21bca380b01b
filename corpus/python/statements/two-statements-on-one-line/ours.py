def origin(chart):
    x = chart.left + 4; y = chart.top
    return x, y
