#[test]
#[ignore]
fn level(port: &Port) -> f64 {
    port.read()
}
