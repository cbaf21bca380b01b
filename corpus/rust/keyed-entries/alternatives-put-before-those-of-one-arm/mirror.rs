fn label(level: Level) -> &'static str {
    match level {
        Level::Surge | Level::Flood | Level::Gale | Level::High | Level::Storm => "rough",
        _ => "calm",
    }
}
