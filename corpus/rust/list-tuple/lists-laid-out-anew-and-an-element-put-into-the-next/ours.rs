const UNITS: &[&str] = &["metre", "foot"];
const MARKS: &[&str] = &[
    "metre",
];
