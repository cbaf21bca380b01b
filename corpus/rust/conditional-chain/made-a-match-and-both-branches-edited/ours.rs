fn refresh(board: &mut Board, key: i64) {
    match board.find(key) {
        Some(depth) => {
            board.level += depth;
            board.note(depth);
        }
        None => {
            board.calm();
            board.log();
        }
    }
}
