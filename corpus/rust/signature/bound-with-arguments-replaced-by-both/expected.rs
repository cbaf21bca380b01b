<<<<<<< ours
pub struct Lazy<F: FnOnce(Port) -> Tide> {
=======
pub struct Lazy<F: Fn(Port) -> Level> {
>>>>>>> theirs
    read: F,
}
