fn check(station: &Station) {
    assert!(low(station) + margin == spring);
    println!("{} {}", level + 1, rate);
}
