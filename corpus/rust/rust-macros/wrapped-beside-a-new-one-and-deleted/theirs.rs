tide_types! {
    note(39, 11);
    pub struct Gauge {
        pub level: Level,
    }

}
