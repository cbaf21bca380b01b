fn publish(board: &mut Board, limit: i64) -> i64 {
    let depth = board.depth();
    let level = board.level();
    board.note(depth);
    board.total += level * 2;
    level + board.offset
}
