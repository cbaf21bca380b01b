const PORTS: &[&str] = &[
    "north-quay",
    // Dries out.
    "south-lock",
    "west-mole",
];
