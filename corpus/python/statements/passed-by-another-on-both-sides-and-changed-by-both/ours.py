chart.draw()
chart = Chart(
    title="Tides today",
)
