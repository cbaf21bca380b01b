fn check(board: &Board) {
    require!(any(board.tide, board.wind, board.berth));
}
