def refresh(station):
#    levels = page.table
    store(levels)
    levels = parse(page)
