rows = ["board"]
rows += ["gauge", "level"]
