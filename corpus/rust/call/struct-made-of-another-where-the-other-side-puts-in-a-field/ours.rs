pub(crate) struct Gauge {
    pub station: u32,
    #[serde(default)]
    pub day: u32,
    pub datum: u32,
}

impl Gauge {
    fn new(station: u32) -> Self {
        Self { station, day: 3, datum: 4 }
    }
}

fn show() {
    draw(Gauge { station: 1, day: 2, datum: 4 });
}
