pub enum Event {
    High(f64),
    Low(f64),
}
