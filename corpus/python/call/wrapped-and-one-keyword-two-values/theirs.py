def today(series, theme):
    image = render_chart(series, width=720, height=320, theme=theme)
    return image.to_png()
