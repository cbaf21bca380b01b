def refresh(station):
#    levels = page.table
    levels = parse(page)
    store(levels)
