def refresh(station):
    page = fetch(station)
    return parse(page)
