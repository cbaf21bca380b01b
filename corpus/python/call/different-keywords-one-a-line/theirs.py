chart = Chart(
    title="Tides today",
    width=640,
    theme="harbour",
)
chart.draw()
