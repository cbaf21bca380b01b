const PORTS: &[&str] = &[
    "north-quay",
    // Only at spring tide.
    "south-lock",
    "west-mole",
];
