fn publish(board: &mut Board, limit: i64) -> i64 {
    let depth = board.depth();
    let level = board.level();
    board.note(depth);
    board.total += level * 4;
    level + board.offset
}
