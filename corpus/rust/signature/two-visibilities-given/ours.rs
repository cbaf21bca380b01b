pub fn refresh(level: f64) {}
