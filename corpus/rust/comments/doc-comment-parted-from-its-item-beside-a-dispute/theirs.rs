gauge! { north, south, west }
/// What is read from a gauge.
pub trait Reading: Height {
}
