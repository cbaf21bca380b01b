board = Board(folder, db=spec, **options)
