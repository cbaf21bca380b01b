fn board() -> Board {
    Board { port: "dover", height: 320, ..Board::default() }
}
