impl Gauge {
    pub const NAME: keys::Any = keys::Any::new("name", &tides::Board::GAUGE);
}
impl Section for Gauge {
    fn name(&self) -> &str_now {
    }
}
