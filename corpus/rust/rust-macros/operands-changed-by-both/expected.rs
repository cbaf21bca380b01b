fn check(station: &Station) {
<<<<<<< ours
    assert!(low(station) + slack == high);
=======
    assert!(low(station) + margin == spring);
>>>>>>> theirs
    println!("{} {}", level + 2, rate);
}
