fn panels() -> Vec<Panel> {
    vec![
        Panel::new("tides", 12),
        Panel::new("wind", 8),
<<<<<<< ours
        Panel::new("moon", 1),
=======
        Panel::new("surge", 3),
>>>>>>> theirs
    ]
}
