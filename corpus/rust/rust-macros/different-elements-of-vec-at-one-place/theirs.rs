fn panels() -> Vec<Panel> {
    vec![
        Panel::new("tides", 12),
        Panel::new("wind", 8),
        Panel::new("surge", 3),
    ]
}
