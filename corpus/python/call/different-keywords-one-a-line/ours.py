chart = Chart(
    title="Tides today",
    width=640,
    height=320,
)
chart.draw()
