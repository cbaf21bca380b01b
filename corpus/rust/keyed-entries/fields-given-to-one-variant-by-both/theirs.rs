pub enum Reading {
    Missing,
    Level { feet: f64 },
}
