def run(kind):
    if kind == "tide":
        draw()
    elif kind == "wind":
        wind()
    else:
        clear()
    flush()
