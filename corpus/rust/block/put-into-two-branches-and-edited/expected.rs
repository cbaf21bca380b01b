fn announce(board: &mut Board, tide: &Tide) {
<<<<<<< ours
    board.show(tide.name.as_str(), Colour::Red);
=======
    if tide.high {
        board.show(tide.label.as_str(), Colour::Red);
    } else {
        board.show(tide.label.as_str(), Colour::Red);
        board.dim();
    }
>>>>>>> theirs
    board.flush();
}
