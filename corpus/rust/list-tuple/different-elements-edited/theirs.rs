const HOURS: [u8; 3] = [6, 12, 17];
const STATIONS: &[&str] = &[
    "dover",
    "wick-harbour",
];
