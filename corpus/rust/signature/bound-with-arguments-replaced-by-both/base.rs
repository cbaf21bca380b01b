pub struct Lazy<F: Fn() -> Tide> {
    read: F,
}
