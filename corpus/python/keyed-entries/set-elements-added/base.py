SPRINGS = {"dover", "wick"}
