COLUMNS = ["time", "level"] + ["wind", "wave", "swell"]
