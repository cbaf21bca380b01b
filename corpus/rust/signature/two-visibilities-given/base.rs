fn refresh(level: f64) {}
