impl Gauge {
}
impl Section for Gauge {
<<<<<<< ours
    pub const NAME: keys::Any = keys::Any::new("name", &tides::Board::GAUGE);
=======
>>>>>>> theirs
    fn name(&self) -> &str_now {
    }
<<<<<<< ours
    fn keys(&self) -> &[&dyn Key] {
        &[&Self::NAME, depth, &Self::QUAY, &Self::LEVEL]
    }
=======
>>>>>>> theirs
}
