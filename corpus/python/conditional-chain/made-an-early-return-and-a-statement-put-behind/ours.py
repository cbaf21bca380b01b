def run():
    if not ok:
        return
    level = read()
    show(level)
