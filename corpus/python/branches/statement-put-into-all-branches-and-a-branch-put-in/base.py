def run(kind):
    if kind == "tide":
        draw()
    else:
        clear()
    flush()
