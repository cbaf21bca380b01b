def refresh(station):
    page = fetch(station)
    # show(page)
    return parse(page)
