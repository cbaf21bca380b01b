fn panels() -> Vec<Panel> {
    vec![
        Panel::new("tides", 24),
        Panel::new("wind", 8),
    ]
}
