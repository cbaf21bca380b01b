pub enum Event {
    High(f64),
    Low(f64),
    Slack,
    Surge { height: f64, wind: f64 },
}
