pub enum Reading {
    Missing,
    Level { metres: f64 },
}
