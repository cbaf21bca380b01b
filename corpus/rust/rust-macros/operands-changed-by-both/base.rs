fn check(station: &Station) {
    assert!(low(station) + margin == high);
    println!("{} {}", level + 1, trend);
}
