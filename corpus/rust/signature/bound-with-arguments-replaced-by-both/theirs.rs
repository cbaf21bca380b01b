pub struct Lazy<F: Fn(Port) -> Level> {
    read: F,
}
