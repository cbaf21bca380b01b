COLUMNS = ["time", "level"] + ["wind", "wave"]
