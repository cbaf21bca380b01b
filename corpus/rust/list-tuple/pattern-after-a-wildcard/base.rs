fn height(reading: &Reading) -> f64 {
    match reading {
        Reading::At(_) => SURGE,
        Reading::Between(_, _) => 0.5,
    }
}
