fn label(level: Level) -> &'static str {
    match level {
        Level::Storm => "rough",
        _ => "calm",
    }
}
