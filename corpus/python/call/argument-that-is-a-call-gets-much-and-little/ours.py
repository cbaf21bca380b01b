def draw(board, level, rows):
    publish(board.all(zone=find(rows, level, "quay", near=2)), 3)
    board.flush()
