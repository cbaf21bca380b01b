fn low(station: u32) -> u32 {
    fetch(station)
}

struct Gauge {
    station: u32,
}

impl Gauge {
    fn new(station: u32) -> Self {
        Gauge { station }
    }

    fn low(&self, day: u32) -> u32 {
        log!("{}", 3 + self.low(4));
        fetch(self.station, day)
    }
}

fn show() {
    log!("low", low(2));
    draw(Gauge::new(3));
    assert_eq!(1 + low(5), Gauge::new(9).station);
}
