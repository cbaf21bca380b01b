fn publish(board: &mut Board, limit: i64) -> i64 {
    let level = board.level();
    if level > limit + 5 {
        board.raise(level - limit);
    }
    board.total += level * 2;
    board.note(level, limit);
    level + board.offset
}
