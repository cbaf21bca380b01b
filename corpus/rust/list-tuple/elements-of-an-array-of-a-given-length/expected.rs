<<<<<<< ours
const MARKS: [&str; 3] = ["low", "high", "spring"];
=======
const MARKS: [&str; 3] = ["neap", "low", "high"];
>>>>>>> theirs
