fn label(level: Level) -> &'static str {
    match level {
        Level::High | Level::Gale | Level::Surge => "rough",
        _ => "calm",
    }
}
