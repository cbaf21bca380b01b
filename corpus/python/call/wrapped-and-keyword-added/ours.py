def today(series, theme):
    image = render_chart(
        series,
        width=640,
        height=320,
    )
    return image.to_png()
