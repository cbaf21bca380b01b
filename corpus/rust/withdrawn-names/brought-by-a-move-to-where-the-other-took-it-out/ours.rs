impl Gauge {
}
impl Section for Gauge {
    pub const NAME: keys::Any = keys::Any::new("name", &tides::Board::GAUGE);
    fn name(&self) -> &str {
    }
    fn keys(&self) -> &[&dyn Key] {
        &[&Self::NAME, depth, &Self::QUAY, &Self::LEVEL]
    }
}
