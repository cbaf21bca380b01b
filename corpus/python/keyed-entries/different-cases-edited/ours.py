def draw(event):
    match event:
        case High(): return bar(event.height, bold=True)
        case Low(): return line(event.height)
        case _: return None
