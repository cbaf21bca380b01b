version = (4, 0, 0, 0)
