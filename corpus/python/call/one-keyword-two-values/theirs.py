def panel(name, rows):
    page = new_page()
    render(rows, width=720, dpi=2)
    page.close()
