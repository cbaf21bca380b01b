low = 1
