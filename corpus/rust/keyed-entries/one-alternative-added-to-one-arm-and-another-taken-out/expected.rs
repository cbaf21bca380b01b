fn label(level: Level) -> &'static str {
    match level {
<<<<<<< ours
        Level::High | Level::Storm | Level::Surge => "rough",
=======
        Level::High => "rough",
>>>>>>> theirs
        _ => "calm",
    }
}
