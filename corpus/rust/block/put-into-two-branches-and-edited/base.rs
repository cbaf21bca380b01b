fn announce(board: &mut Board, tide: &Tide) {
    board.show(tide.label.as_str(), Colour::Red);
    board.flush();
}
