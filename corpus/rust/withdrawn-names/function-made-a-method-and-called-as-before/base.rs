struct Board {
    level: i64,
}

fn scaled(board: &Board, by: i64) -> i64 {
    board.level * by
}

fn publish(board: &Board) -> i64 {
    scaled(board, 3)
}
