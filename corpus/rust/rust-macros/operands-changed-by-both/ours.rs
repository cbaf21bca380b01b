fn check(station: &Station) {
    assert!(low(station) + slack == high);
    println!("{} {}", level + 2, trend);
}
