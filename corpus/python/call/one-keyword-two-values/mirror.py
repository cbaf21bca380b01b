def panel(name, rows):
    page = new_page()
<<<<<<< ours
    render(rows, width=720, dpi=2, title=name)
=======
    render(rows, width=800, dpi=2, title=name)
>>>>>>> theirs
    page.close()
