fn board() -> Board {
    Board { port: "dover", width: 640, height: 320, ..Board::default() }
}
