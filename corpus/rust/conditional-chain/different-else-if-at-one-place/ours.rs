fn colour(level: f64) -> Colour {
    if level > 5.0 {
        Colour::Red
    } else if level > 4.0 {
        Colour::Orange
    } else {
        Colour::Green
    }
}
