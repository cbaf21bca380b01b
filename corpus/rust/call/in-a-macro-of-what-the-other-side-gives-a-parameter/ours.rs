fn low(station: u32, unit: u32) -> u32 {
    fetch(station)
}

struct Gauge {
    station: u32,
}

impl Gauge {
    fn new(station: u32, datum: u32) -> Self {
        Gauge { station }
    }

    fn low(&self, day: u32, zone: u32) -> u32 {
        log!("{}", 3);
        fetch(self.station, day)
    }
}

fn show() {
    log!("low", low(2, 7));
    draw(Gauge::new(3, 8));
}
