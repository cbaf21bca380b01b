gauge! {
    /// The level of the water.
    fn level(port: Port) -> f64;
}

gauge! {
    /// The temperature of the water.
    fn temperature(port: Port) -> f64;
}
