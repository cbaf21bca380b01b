fn publish(board: &mut Board) -> i64 {
    let depth = board.depth();
    {
        board.log();
        board.level += 2;
        board.send();
    }
    depth
}
