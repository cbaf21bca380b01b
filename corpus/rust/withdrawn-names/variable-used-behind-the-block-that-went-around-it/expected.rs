fn high(station: u32) -> f64 {
    fetch(station).max()
}

fn low(station: u32) -> f64 {
    if open(station) {
        let levels = fetch(station);
        draw(station);
    }
<<<<<<< ours
    levels.min()
=======
    0.0
>>>>>>> theirs
}
