fn label(level: Level) -> &'static str {
    match level {
        Level::Flood | Level::Gale | Level::Surge | Level::High | Level::Storm => "rough",
        _ => "calm",
    }
}
