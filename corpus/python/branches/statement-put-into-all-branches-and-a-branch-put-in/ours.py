def run(kind):
    if kind == "tide":
        draw()
        flush()
    else:
        clear()
        flush()
