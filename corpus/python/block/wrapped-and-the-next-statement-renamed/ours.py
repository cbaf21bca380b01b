def refresh(station):
    if station.online:
        page = fetch(station)
#    rows = page.table
    levels = parse(page)
    store(levels)
