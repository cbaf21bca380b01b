def read(page):
    rows = [parse(page)]
    return ([rows, page.title, page.unit], None)
