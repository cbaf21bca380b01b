fn publish(board: &mut Board) {
    if board.open {
        board.log();
<<<<<<< ours
=======
        let depth = board.depth();
>>>>>>> theirs
        board.level += depth;
        board.send();
    }
    board.close();
    board.note(depth);
}
