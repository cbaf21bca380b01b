const MARKS: [&str; 2] = ["ebb", "high"];
