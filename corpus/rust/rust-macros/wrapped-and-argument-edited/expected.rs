#[test]
fn feet() {
    assert_eq!(
        metres(10.0, Unit::Feet),
        3.048_f64,
        "ten feet"
    );
}
