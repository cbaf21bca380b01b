const UNITS: &[&str] = &["metre"];
const MARKS: &[&str] = &[
    "metre",
    "foot",
];
