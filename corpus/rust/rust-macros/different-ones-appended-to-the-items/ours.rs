gauge! {
    /// The level of the water.
    fn level(port: Port) -> f64;
}

gauge! {
    /// How fast the water runs, in knots.
    fn current(port: Port, depth: f64) -> f64;
}
