def today(series, theme):
    image = render_chart(
        series,
        theme,
        width=640,
        height=320,
    )
    return image.to_png()
