struct Gauge {
    depth: u32,
}

impl Gauge {
    fn low(&self) -> u32 {
        draw(1);
<<<<<<< ours
=======
        log!("{}", self.level);
>>>>>>> theirs
        self.depth
    }
}
