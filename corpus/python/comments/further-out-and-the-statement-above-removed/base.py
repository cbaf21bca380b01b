def refresh(station):
    page = fetch(station)
#    rows = page.table
    rows = parse(page)
    show(rows, 1)
