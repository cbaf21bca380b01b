def panel(name, rows):
    page = new_page()
<<<<<<< ours
    render(rows, width=800, title=name, dpi=2)
=======
    render(rows, width=720, title=name, dpi=2)
>>>>>>> theirs
    page.close()
