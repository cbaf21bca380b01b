chart.draw()
chart = Chart(
    title="Tides today",
    width_of_all=640,
)
