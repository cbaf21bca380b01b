fn colour(level: f64) -> Colour {
    if level > 5.0 {
        Colour::Crimson
    } else {
        Colour::Green
    }
}
