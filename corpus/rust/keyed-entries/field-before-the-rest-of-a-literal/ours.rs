fn board() -> Board {
    Board { port: "dover", width: 640, ..Board::default() }
}
