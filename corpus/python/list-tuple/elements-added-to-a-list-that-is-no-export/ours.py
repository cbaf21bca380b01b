rows = ["board"]
rows += ["gauge", "level", "port"]
