fn check(board: &Board) {
<<<<<<< ours
    require!(any(board.tide, board.wind, board.berth));
=======
    require!(any(board.tide, board.wind, board.fog));
>>>>>>> theirs
}
