def draw(event):
    match event:
        case High(): return bar(event.height)
        case Low(): return line(event.height)
        case _: return None
