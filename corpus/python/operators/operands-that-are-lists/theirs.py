COLUMNS = ["time", "height"] + ["wind", "wave", "swell"]
