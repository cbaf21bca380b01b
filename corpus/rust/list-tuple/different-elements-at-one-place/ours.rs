const HOURS: [u8; 3] = [6, 12, 18];
const STATIONS: &[&str] = &[
    "dover",
    "wick-harbour",
    "oban",
];
