fn board() -> Board {
    Board { port: "dover", theme: Theme::Night, rows: vec![], height: 320, width: 640 }
}
