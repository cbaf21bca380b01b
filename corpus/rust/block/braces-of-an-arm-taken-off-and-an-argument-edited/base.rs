fn draw(level: Level) -> Line {
    match level {
        Level::High => {
            line(level, "high", 2)
        },
        _ => plain(),
    }
}
