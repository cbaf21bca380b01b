pub enum Event {
    High(f64),
    Low(f64),
    Surge { height: f64, wind: f64 },
}
