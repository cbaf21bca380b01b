fn height(reading: &Reading) -> f64 {
    match reading {
        Reading::At(_, surge) => SURGE,
        Reading::Between(first, _) => 0.5,
    }
}
