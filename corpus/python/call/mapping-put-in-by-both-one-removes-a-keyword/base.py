board = Board(folder, db=spec)
