const HOURS: [u8; 3] = [5, 12, 18];
const STATIONS: &[&str] = &[
    "dover-pier",
    "wick",
];
