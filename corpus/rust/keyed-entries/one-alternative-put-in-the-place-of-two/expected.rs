fn label(level: Level) -> &'static str {
    match level {
<<<<<<< ours
        Level::Gale | Level::Storm | Level::Surge => "rough",
=======
        Level::High | Level::Gale | Level::Surge => "rough",
>>>>>>> theirs
        _ => "calm",
    }
}
