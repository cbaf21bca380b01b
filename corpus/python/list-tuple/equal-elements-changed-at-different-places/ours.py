version = (4, 1, 0, 7)
