fn publish(board: &mut Board, limit: i64) -> i64 {
    let depth = board.level();
    if depth > limit + 3 {
        board.raise(depth - limit);
    }
    board.total += depth * 2;
    depth + board.offset
}

fn settle(board: &mut Board) -> i64 {
    let depth = board.depth();
    board.note(depth);
    depth * 3
}
