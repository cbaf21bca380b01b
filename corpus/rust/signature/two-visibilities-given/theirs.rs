pub(crate) fn refresh(level: f64) {}
