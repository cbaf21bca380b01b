def draw(event):
    match event:
        case High(): return bar(event.height, bold=True)
        case Low(): return line(event.height, dash=2)
        case _: return None
