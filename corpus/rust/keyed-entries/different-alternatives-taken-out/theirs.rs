fn label(level: Level) -> &'static str {
    match level {
        Level::High | Level::Surge => "rough",
        _ => "calm",
    }
}
