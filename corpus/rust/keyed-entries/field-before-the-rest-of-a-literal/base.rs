fn board() -> Board {
    Board { port: "dover", ..Board::default() }
}
