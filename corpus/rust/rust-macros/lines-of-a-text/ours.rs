#[test]
fn renders() {
    assert_eq!(
        render(&tide()),
        r#"station = "quay"
height = 4
unit = "m"
"#
    );
}
