const MARKS: [&str; 2] = ["low", "high"];
