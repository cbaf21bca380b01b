def show(rows):
    draw(1)
    save(2)
