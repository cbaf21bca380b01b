fn risky(level: f64, wind: u8) -> bool {
<<<<<<< ours
    warn(level > 5.0 && wind > 6, Channel::All)
=======
    warn(level > 4.0 && wind >= 8, Channel::All)
>>>>>>> theirs
}
