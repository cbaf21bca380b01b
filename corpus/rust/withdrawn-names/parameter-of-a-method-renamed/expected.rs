fn weight() -> i64 {
    31
}

impl Board {
    fn note(&mut self, by: i64, pull: i64) {
        let lamp = by % 7;
        self.lamp = lamp;
        if self.gauge > 26 {
            self.tide = pull;
<<<<<<< ours
=======
        } else {
            self.tide = weight + 2;
>>>>>>> theirs
        }
        self.flow += by * pull;
    }
}
