def refresh(station):
    if station.online:
        page = fetch(station)
    log.debug("fetched %s", station)
#    rows = page.table
    levels = parse(page, strict=True)
    store(levels)
