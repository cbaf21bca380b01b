const HOURS: [u8; 3] = [5, 12, 17];
const STATIONS: &[&str] = &[
    "dover-pier",
    "wick-harbour",
];
