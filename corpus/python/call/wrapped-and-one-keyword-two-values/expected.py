def today(series, theme):
    image = render_chart(
        series,
<<<<<<< ours
        width=800,
=======
        width=720,
>>>>>>> theirs
        height=320,
        theme=theme,
    )
    return image.to_png()
