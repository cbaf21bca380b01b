version = (4, 1, 1, 7)
