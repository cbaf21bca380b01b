struct Board {
    level: i64,
}

fn scaled(board: &Board, by: i64) -> i64 {
    board.level * by
}

fn publish(board: &Board) -> i64 {
    log(scaled(board, 1));
    scaled(board, 3)
}
