fn announce(board: &mut Board, tide: &Tide) {
    board.show(tide.name.as_str(), Colour::Red);
    board.flush();
}
