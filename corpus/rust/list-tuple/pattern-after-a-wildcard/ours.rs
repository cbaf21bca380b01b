fn height(reading: &Reading) -> f64 {
    match reading {
        Reading::At(_, height) => SURGE,
        Reading::Between(_, _, weight) => 0.5,
    }
}
