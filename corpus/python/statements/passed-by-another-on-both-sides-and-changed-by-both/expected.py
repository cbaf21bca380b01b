chart.draw()
chart = Chart(
    title="Tides today",
<<<<<<< ours
=======
    width_of_all=640,
>>>>>>> theirs
)
