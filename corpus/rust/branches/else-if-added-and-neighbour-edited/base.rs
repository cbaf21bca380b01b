fn colour(level: f64) -> Colour {
    if level > 5.0 {
        Colour::Red
    } else {
        Colour::Green
    }
}
