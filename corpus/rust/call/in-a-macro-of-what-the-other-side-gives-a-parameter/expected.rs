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
<<<<<<< ours
        log!("{}", 3);
=======
        log!("{}", 3 + self.low(4));
>>>>>>> theirs
        fetch(self.station, day)
    }
}

fn show() {
    log!("low", low(2, 7));
    draw(Gauge::new(3, 8));
<<<<<<< ours
=======
    assert_eq!(1 + low(5), Gauge::new(9).station);
>>>>>>> theirs
}
