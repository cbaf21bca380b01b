#[test]
fn feet() {
    assert_eq!(
        metres(10.0, Unit::Feet),
        3.048,
        "ten feet"
    );
}
