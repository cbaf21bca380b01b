def show(rows):
    levels = [row.level for row in rows]
    log(levels)
    draw(1, ports=[row.port for row in rows])
    save(2)
