#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn feet_become_metres() {
        assert_eq!(metres(10.0, Unit::Feet), 3.048);
    }

    #[test]
    fn metres_stay() {
        assert_eq!(metres(1.5, Unit::Metres), 1.5);
    }
}
