fn board() -> Board {
    Board { port: "dover", height: 320, width: 640, ..Board::default() }
}
