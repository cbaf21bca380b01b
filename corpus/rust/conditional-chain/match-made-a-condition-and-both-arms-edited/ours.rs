fn refresh(board: &mut Board, key: i64) {
    if let Some(depth) = board.find(key) {
        board.level += depth;
        board.note(depth);
    } else {
        board.calm();
        board.log();
    }
}
