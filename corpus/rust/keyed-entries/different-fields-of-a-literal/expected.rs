fn board() -> Board {
    Board { port: "dover", theme: Theme::Night, rows: vec![], width: 640, height: 320 }
}
