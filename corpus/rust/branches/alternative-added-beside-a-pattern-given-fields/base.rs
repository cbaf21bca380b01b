pub fn name(reading: &Reading) -> &str {
    match reading {
        Reading::Lost => "lost",
        Reading::Level(_) => "level",
    }
}
