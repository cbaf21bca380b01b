fn label(level: Level) -> &'static str {
    match level {
        Level::High => "rough",
        _ => "calm",
    }
}
