pub trait Feed {
    fn poll(&mut self) -> Line;

    fn name(&self) -> &str {
        "feed"
    }
}
