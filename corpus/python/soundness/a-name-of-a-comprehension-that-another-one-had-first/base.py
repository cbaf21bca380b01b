def show(rows):
    levels = [row.level for row in rows]
    log(levels)
    draw(1)
    save(2)
