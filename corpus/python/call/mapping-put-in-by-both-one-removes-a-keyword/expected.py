board = Board(folder, **options)
