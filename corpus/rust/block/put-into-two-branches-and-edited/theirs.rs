fn announce(board: &mut Board, tide: &Tide) {
    if tide.high {
        board.show(tide.label.as_str(), Colour::Red);
    } else {
        board.show(tide.label.as_str(), Colour::Red);
        board.dim();
    }
    board.flush();
}
