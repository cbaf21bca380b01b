SPRINGS = {"dover", "wick", "oban", "leith"}
