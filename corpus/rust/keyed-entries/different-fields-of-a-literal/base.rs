fn board() -> Board {
    Board { port: "dover", theme: Theme::Day, rows: vec![] }
}
