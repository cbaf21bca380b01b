fn label(level: Level) -> &'static str {
    match level {
        Level::Gale | Level::Storm | Level::Surge => "rough",
        _ => "calm",
    }
}
