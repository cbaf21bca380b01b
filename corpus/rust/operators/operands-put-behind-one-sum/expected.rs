fn total(low: f64) -> f64 {
<<<<<<< ours
    low + 1.0 + SWELL
=======
    low + 1.0 + WIND
>>>>>>> theirs
}
