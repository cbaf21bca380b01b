#[test]
fn renders() {
    assert_eq!(
        render(&tide()),
        r#"station = "quay"
height = 3
unit = "m"
"#
    );
}
