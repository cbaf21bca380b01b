impl Gauge {
    pub const NAME: keys::Any = keys::Any::new("name", &tides::Board::GAUGE);
}
impl Section for Gauge {
    fn name(&self) -> &str {
    }
    fn keys(&self) -> &[&dyn Key] {
        &[&Self::NAME, &Self::QUAY, &Self::LEVEL]
    }
}
