fn label(level: Level) -> &'static str {
    match level {
        Level::Flood(Stage::Late) | Level::Gale | Level::Surge => "rough",
        _ => "calm",
    }
}
