impl Tide {
    fn label(self) -> &'static str {
        match self {
            Self::Low => "low water",
            Self::Rising => "rising",
            Self::High => "high water",
        }
    }
}
