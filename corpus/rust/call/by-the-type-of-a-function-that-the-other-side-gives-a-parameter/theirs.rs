struct Gauge {
    station: u32,
}

impl Gauge {
    fn new(station: u32) -> Self {
        Gauge { station }
    }

    fn low(&self, day: u32) -> u32 {
        fetch(self.station, day)
    }
}

fn show(station: u32) {
    draw(Gauge::new(station).low(2));
    draw(Gauge::new(station + 1).low(3));
}
