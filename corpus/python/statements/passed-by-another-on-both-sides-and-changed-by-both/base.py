chart = Chart(
    title="Tides today",
    width=640,
)
chart.draw()
