COLUMNS = ["time", "height"] + ["wind", "wave"]
