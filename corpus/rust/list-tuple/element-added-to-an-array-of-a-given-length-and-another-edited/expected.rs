const MARKS: [&str; 3] = ["ebb", "high", "spring"];
