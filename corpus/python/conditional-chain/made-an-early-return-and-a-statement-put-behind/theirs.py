def run():
    if ok:
        level = read()
        show(level)
    close()
