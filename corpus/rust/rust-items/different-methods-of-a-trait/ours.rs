pub trait Feed {
    fn poll(&mut self) -> Line;

    fn reset(&mut self);
}
