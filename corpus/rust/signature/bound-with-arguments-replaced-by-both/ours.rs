pub struct Lazy<F: FnOnce(Port) -> Tide> {
    read: F,
}
