tide_types! {
    note(40, 11);
    pub struct Gauge {
        pub level: Level,
    }
    let port = harbour(39);

<<<<<<< ours
    if metric {
        pub union Level {
            pub metres: f32,
            pub feet: u32,
        }
    }
=======
>>>>>>> theirs
}
