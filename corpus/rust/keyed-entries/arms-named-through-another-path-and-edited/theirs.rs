impl Tide {
    fn label(self) -> &'static str {
        match self {
            Tide::Low => "low water",
            Tide::Rising => "rising",
            Tide::High => "high water",
        }
    }
}
