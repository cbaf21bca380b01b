use tides::levels::Level;

fn high(level: Level) -> bool {
    level.metres > 3.0
}

fn low(level: Level) -> bool {
    level.metres < 1.0
}
