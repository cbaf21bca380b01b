const DAYS: usize = 4;

/// The levels of one station, as the gauge tells them.

pub struct Levels {
    rows: Vec<f64>,
}
