SPRINGS = {"dover", "wick", "leith"}
