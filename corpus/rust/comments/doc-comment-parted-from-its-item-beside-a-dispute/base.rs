gauge! { north, south, east }
/// What is read from a gauge.
pub trait Reading: Level {
}
