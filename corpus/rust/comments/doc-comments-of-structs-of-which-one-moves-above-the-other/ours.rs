pub mod levels {
    #[derive(Debug, Clone, Copy)]
    pub struct Series<T>(T);
    #[derive(Debug, Clone, Copy)]
    pub struct Height;
    #[derive(Debug, Clone, Copy)]
    pub struct Storm;

    pub type Metres = f64;
}
