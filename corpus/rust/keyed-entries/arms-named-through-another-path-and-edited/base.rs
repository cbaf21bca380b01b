impl Tide {
    fn label(self) -> &'static str {
        match self {
            Tide::Low => "low",
            Tide::Rising => "rising",
            Tide::High => "high",
        }
    }
}
