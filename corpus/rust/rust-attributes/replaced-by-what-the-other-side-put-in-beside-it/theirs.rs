#[ignore]
fn level(port: &Port, unit: Unit) -> f64 {
    port.read(unit)
}
