def refresh(station):
    with lock:
        page = fetch(station)
#    rows = page.table
        rows = parse(
            page, unit='m')
        store(rows)
    return rows
