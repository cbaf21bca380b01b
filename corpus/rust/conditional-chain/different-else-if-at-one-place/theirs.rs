fn colour(level: f64) -> Colour {
    if level > 5.0 {
        Colour::Crimson
    } else if level > 3.0 {
        Colour::Yellow
    } else {
        Colour::Green
    }
}
