gauge! {
    /// The level of the water.
    fn level(port: Port) -> f64;
}
