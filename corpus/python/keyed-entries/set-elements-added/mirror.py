SPRINGS = {"dover", "wick", "leith", "oban"}
