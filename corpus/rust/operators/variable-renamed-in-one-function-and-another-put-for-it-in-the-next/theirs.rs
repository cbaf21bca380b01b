fn publish(board: &mut Board, limit: i64) -> i64 {
    let level = board.level();
    if level > limit + 3 {
        board.raise(level - limit);
    }
    board.total += level * 2;
    level + board.offset
}

fn settle(board: &mut Board) -> i64 {
    let depth = board.depth();
    let level = board.level();
    board.note(depth);
    level * 4
}
