const PORTS: &[&str] = &[
    "north-quay",
    "south-lock",
    "west-mole",
];
