fn label(level: Level) -> &'static str {
    match level {
        Level::High | Level::Storm => "rough",
        _ => "calm",
    }
}
