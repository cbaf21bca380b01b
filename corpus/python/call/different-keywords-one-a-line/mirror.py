chart = Chart(
    title="Tides today",
    width=640,
    theme="harbour",
    height=320,
)
chart.draw()
