def draw(board, level, rows):
    publish(board.all(unit="m", zone=find(rows, level, "quay", near=2)), 3)
    board.flush()
