pub fn name(reading: &Reading) -> &str {
    match reading {
        Reading::Lost | Reading::Late => "lost",
        Reading::Level(_) => "level",
    }
}
