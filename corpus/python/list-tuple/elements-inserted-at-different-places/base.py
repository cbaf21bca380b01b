hours = [6, 12, 18]
