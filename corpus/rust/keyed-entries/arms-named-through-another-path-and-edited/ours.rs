impl Tide {
    fn label(self) -> &'static str {
        match self {
            Self::Low => "low",
            Self::Rising => "rising",
            Self::High => "high",
        }
    }
}
