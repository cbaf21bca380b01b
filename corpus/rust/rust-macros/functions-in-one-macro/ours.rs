gauges! {
    fn low(level: f32, datum: f32) { check(level, 1) }
    fn high(level: f32) { check(level, 4) }
}
