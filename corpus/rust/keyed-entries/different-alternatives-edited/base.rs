fn label(level: Level) -> &'static str {
    match level {
        Level::High | Level::Storm | Level::Surge => "rough",
        _ => "calm",
    }
}
