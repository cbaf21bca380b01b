def show(rows):
    draw(1, ports=[row.port for row in rows])
    save(2)
