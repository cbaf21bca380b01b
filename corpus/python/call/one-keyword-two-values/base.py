def panel(name, rows):
    page = new_page()
    render(rows, width=640)
    page.close()
