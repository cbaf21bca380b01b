fn height(reading: &Reading) -> f64 {
    match reading {
<<<<<<< ours
        Reading::At(_, height) => SURGE,
=======
        Reading::At(_, surge) => SURGE,
>>>>>>> theirs
        Reading::Between(first, _, weight) => 0.5,
    }
}
