def refresh(station):
    page = fetch(station) #the newest, or the last
    return parse(page)
