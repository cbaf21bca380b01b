const MARKS: [&str; 3] = ["low", "high", "spring"];
