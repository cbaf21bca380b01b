def refresh(station):

#    rows = page.table
    rows = parse(station)
    show(rows, 2)
