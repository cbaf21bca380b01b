SPRINGS = {"dover", "wick", "oban"}
