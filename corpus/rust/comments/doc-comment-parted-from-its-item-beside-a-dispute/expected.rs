<<<<<<< ours
=======
gauge! { north, south, west }
>>>>>>> theirs
/// What is read from a gauge.

pub trait Reading: Height {
}
