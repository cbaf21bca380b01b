pub mod levels {
    #[derive(Debug, Clone, Copy)]
    pub struct Height;
    #[derive(Debug, Clone, Copy)]
    pub struct Series<T>(T);
    pub type Metres = f64;
}
