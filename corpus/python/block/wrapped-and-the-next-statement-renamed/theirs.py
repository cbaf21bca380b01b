def refresh(station):
    page = fetch(station)
    log.debug("fetched %s", station)
#    rows = page.table
    rows = parse(page, strict=True)
    store(rows)
