fn risky(level: f64, wind: u8) -> bool {
    warn(level > 4.0 && wind > 6, Channel::Radio)
}
