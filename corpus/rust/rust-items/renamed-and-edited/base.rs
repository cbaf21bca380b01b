fn conv(height: f64, unit: Unit) -> f64 {
    let factor = unit.factor();
    height * factor
}
