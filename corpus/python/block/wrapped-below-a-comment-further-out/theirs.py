def refresh(station):
    with lock:
        page = fetch(station)
#    rows = page.table
        rows = parse(
            page)
        store(rows)
    return rows
