pub enum Reading {
    Missing,
    Level,
}
