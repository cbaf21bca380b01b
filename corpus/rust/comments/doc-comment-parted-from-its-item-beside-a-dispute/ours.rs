/// What is read from a gauge.

pub trait Reading: Level {
}
