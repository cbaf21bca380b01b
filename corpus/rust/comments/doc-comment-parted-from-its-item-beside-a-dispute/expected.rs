<<<<<<< ours
/// What is read from a gauge.

=======
gauge! { north, south, west }
/// What is read from a gauge.
>>>>>>> theirs
pub trait Reading: Height {
}
