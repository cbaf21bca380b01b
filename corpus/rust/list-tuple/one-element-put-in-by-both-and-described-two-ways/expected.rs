const PORTS: &[&str] = &[
    "north-quay",
<<<<<<< ours
    // Dries out.
=======
    // Only at spring tide.
>>>>>>> theirs
    "south-lock",
    "west-mole",
];
