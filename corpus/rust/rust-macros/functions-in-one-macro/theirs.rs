gauges! {
    fn low(level: f32) { check(level, 1) }
    fn high(level: f32) -> Flood { check(level, 4) }
}
