const MARKS: [&str; 3] = ["neap", "low", "high"];
