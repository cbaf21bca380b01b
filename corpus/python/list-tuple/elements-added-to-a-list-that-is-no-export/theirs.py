rows = ["board"]
rows += ["gauge", "level", "chart"]
