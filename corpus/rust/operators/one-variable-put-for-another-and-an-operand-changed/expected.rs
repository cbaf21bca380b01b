fn publish(board: &mut Board, limit: i64) -> i64 {
    let depth = board.depth();
    board.note(depth);
<<<<<<< ours
    board.total += depth * 2;
=======
    board.total += level * 4;
>>>>>>> theirs
    depth + board.offset
}
