pub mod levels {
    /// A height above the chart datum.
    ///
    /// Measured by the gauge at the quay.
    #[derive(Debug, Clone, Copy)]
    pub struct Height;

    /// Readings in the order in which they were taken.
    #[derive(Debug, Clone, Copy)]
    pub struct Series<S>(S);

    /// Metres, as the pilots want them.
    pub type Metres = f64;
}
