fn label(level: Level) -> &'static str {
    match level {
        Level::Surge | Level::High | Level::Storm => "rough",
        _ => "calm",
    }
}
