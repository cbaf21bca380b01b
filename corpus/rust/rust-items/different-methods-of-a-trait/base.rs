pub trait Feed {
    fn poll(&mut self) -> Line;
}
