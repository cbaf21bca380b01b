def refresh(station):
    store(levels)
#    levels = page.table
    levels = parse(page)
