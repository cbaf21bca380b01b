def today(series, theme):
    image = render_chart(
        series,
        width=800,
        height=320,
    )
    return image.to_png()
