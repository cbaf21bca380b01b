fn label(level: Level) -> &'static str {
    match level {
<<<<<<< ours
        Level::High => "rough",
=======
        Level::Storm => "rough",
>>>>>>> theirs
        _ => "calm",
    }
}
