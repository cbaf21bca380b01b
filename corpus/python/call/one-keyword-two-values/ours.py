def panel(name, rows):
    page = new_page()
    render(rows, width=800, title=name)
    page.close()
