version = (4, 0, 1, 7)
