fn label(level: Level) -> &'static str {
    match level {
        Level::Flood(Stage::Late) | Level::Storm | Level::Surge => "rough",
        _ => "calm",
    }
}
