pub fn name(reading: &Reading) -> &str {
    match reading {
        Reading::Lost(_) => "lost",
        Reading::Level(_) => "level",
    }
}
