<<<<<<< ours
#[derive(Clone, Debug)]
pub struct Gauge {
    pub level: i64,
    pub name: String,
}

=======
#[derive(Debug)]
pub struct Gauge {
    pub level: i64,
    pub name: String,
}

impl Clone for Gauge {
    fn clone(&self) -> Self {
        Gauge { level: self.level, name: self.name.clone() }
    }
}

>>>>>>> theirs
pub fn read(gauge: &Gauge) -> i64 {
    gauge.level
}
