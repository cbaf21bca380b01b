fn colour(level: f64) -> Colour {
    if level > 5.0 {
        Colour::Crimson
<<<<<<< ours
    } else if level > 4.0 {
        Colour::Orange
=======
    } else if level > 3.0 {
        Colour::Yellow
>>>>>>> theirs
    } else {
        Colour::Green
    }
}
