fn panels() -> Vec<Panel> {
    vec![
        Panel::new("tides", 12),
        Panel::new("wind", 6),
    ]
}
