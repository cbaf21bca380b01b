def refresh(station):
    page = fetch(station) # the newest
    return parse(page)
