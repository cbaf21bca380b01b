fn publish(board: &mut Board, limit: i64) -> i64 {
    let depth = board.depth();
    board.note(depth);
    board.total += depth * 2;
    depth + board.offset
}
