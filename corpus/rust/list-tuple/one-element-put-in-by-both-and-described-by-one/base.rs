const PORTS: &[&str] = &[
    "north-quay",
    "west-mole",
];
