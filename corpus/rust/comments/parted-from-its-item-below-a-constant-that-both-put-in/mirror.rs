const DAYS: usize = 4;

const ROWS: usize = 61;

/// The levels of one station, as the gauge tells them.

// Of the quayside box.
pub struct Levels {
    rows: Vec<f64>,
}
