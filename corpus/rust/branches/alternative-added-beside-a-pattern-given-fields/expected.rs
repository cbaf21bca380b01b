pub fn name(reading: &Reading) -> &str {
    match reading {
        Reading::Lost(_) | Reading::Late => "lost",
        Reading::Level(_) => "level",
    }
}
