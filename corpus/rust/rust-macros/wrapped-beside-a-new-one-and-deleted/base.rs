tide_types! {
    note(39, 10);
    pub struct Gauge {
        pub level: Level,
    }

    pub union Level {
        pub metres: f32,
        pub feet: u32,
    }
}
