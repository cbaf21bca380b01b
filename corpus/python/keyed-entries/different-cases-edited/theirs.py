def draw(event):
    match event:
        case High(): return bar(event.height)
        case Low(): return line(event.height, dash=2)
        case _: return None
